import { createRoot } from 'react-dom/client';
import { openStore } from '../record';
import { App } from './app';
import './styles/theme.css';
import './styles/bedside.css';
import './styles/desk.css';

const page = document.getElementById('page') as HTMLElement;
const { store, notice } = await openStore();
createRoot(page).render(<App store={store} notice={notice} />);
